"""A day put together: course, belief, plan, history and seed become guide, pages, key and prep list."""
