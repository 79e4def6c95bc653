"""Timber: species and their values, moisture, density, movement, climates, and measured stock."""
