"""What crops yield: by tray, batch, shelf and slot; what batches are out of the usual."""
