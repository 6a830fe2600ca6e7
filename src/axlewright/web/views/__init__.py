"""What the pages show, made from reports: plain values that templates only lay out."""
