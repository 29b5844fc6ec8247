"""What authors start from and upgrade with; loaded only when asked for."""
