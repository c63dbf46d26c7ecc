"""Who gets what and when: customers, mixes, orders, deliveries and what covers them."""
