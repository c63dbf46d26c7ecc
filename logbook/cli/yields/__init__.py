"""Commands about yields and costs."""
