"""What the maker's manual and the job sheet say, as records in SI."""
