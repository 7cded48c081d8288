"""Physics of rope, tackle, drum and boom on plain SI floats."""
