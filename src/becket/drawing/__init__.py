"""Pictures of reeving, changes and plans as records, and as SVG text."""
