"""Labels for winders, wallets and drawers, and the papers they come on."""
