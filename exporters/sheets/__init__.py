"""Shop drawings: a piece's parts and views laid out on paper, dimensioned, and written as DXF."""
