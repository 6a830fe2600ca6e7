"""Pictures and charts as data: immutable shapes in millimeters, and what turns them into SVG."""
