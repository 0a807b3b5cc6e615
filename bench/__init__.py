"""Speed, measured as ratios in one run on the same work. See `RECORD.md` beside this file for how to read it."""
