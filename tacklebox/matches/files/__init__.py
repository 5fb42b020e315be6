"""What an angler writes of a match: the match, its venue, its feed."""
