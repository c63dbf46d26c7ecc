"""Programs run by hand that measure what the code promises."""
