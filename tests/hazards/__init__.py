"""Dangerous and sound pieces of others' making, each with its source, put through the tool."""
