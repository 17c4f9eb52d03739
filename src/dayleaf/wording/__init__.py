"""An item or a picture said in a language: sentences, plurals, units, names of numbers.

What other rooms call (`lang` is "en" or "es"; every function raises `NoWords` when a code has no
words, and `NotInThisLanguage` when a skill has none in that language):

- `say.text_of(item, lang) -> str` one plain line: "62 − 38 = □", a question with its options, a story
- `say.lines_of(item, lang) -> tuple[str, ...]` the sentences a child reads, one a line
- `say.steps_of(item, lang) -> tuple[str, ...]` the steps of the key
- `say.option_words(code, lang, item=None) -> str` one option; a numeral stays as it is
- `say.word_of(code, lang, count=None) -> str` a word of a row ("ten", "tens")
- `instructions.instruction_for(item, lang) -> str`, `instructions.instruction_for_many(items, lang) -> str`
- `pictures.figure_words(figure, lang) -> tuple[str, str]` title and description, for `figures.draw`
- `pictures.figure_texts(figure, lang) -> dict[str, str]` code -> word, for `figures.draw(words=…)`
- `numbers.number_name(n, lang) -> str` 0 … 9999
- `nouns.noun(code, lang) -> Noun(one, many, gender)`, `nouns.counted(n, code, lang)`, `nouns.with_article(code, lang)`
- `ways.way_phrase(error_way, lang) -> str`, `ways.try_next(error_way, lang) -> str`
- `page.page_word(code, lang) -> str` furniture of a page: Name, Date, Say, Do …
- `languages.languages_of(skill) -> tuple[str, ...]`, `languages.check_language(skill, lang)`
"""
