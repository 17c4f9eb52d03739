"""Problems: rule -> numbers -> answer with steps; a second solver; error ways. No sentence lives here."""
