"""The checks told to a maker: on paper (`write`) and on the terminal (`terminal`)."""
