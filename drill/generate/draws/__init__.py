"""What differs from one student to the next, drawn from a stream of our own."""
