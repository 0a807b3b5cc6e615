"""The commands, one a file; `cli/main.py` lists them."""
