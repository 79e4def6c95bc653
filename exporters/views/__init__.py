"""Views: solids projected to plain lines and arcs, at 1:1, knowing nothing of paper."""
