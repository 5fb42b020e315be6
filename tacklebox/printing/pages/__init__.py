"""Pages: tie sheet, pack list, shopping list."""
