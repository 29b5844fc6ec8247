"""Every key an author may write, described once: for checking and for the guide."""
