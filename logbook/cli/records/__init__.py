"""Commands about records that rules ask for."""
