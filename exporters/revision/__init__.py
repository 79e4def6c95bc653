"""What a change of the design makes of the parts that are cut: on the screen, sheets, as data."""
