"""Classical cutting problems in whole numbers: one board's best value, fewest equal boards, bars.

The planner's neighbours, for orders without matches: sizes are whole numbers of any unit, kerf
already added to parts and boards alike.
"""
