"""The week's rules: a family a file, each a function from what the week asks for to rows over its days."""
