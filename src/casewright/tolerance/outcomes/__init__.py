"""What each gap and each case comes out as."""
