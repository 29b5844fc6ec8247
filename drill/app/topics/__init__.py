"""Topic decks: made, checked, tried and handed out."""
