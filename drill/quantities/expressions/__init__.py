"""The formula language: text to tokens, tokens to a small syntax tree, and back to text."""
