"""Charts: data in, an Altair chart out; no chart asks what is on the page."""
