"""Words → every reading of the number they may be, ranked."""
