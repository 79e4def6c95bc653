"""What is checked against the outside world: published values and general-purpose libraries."""
