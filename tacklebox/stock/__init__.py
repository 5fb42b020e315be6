"""Tackle in stock: tables, the ledger, one-line notation, CSV."""
