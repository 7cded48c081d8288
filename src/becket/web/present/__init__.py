"""What a page says, worked out from records before it is written into a template."""
