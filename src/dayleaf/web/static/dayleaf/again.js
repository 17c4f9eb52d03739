// See it again: the device reads a step aloud, and the arrow keys turn the pages. Without this file links do the same.
"use strict";
const sheet = document.querySelector("[data-again]");
const button = sheet?.querySelector("[data-aloud]");
if (button && "speechSynthesis" in window) {
  button.hidden = false;
  button.addEventListener("click", () => {
    speechSynthesis.cancel();
    const said = new SpeechSynthesisUtterance(sheet.querySelector("[data-words]").textContent.replaceAll("□", "what?"));
    said.lang = "en";
    said.rate = 0.85;
    speechSynthesis.speak(said);
  });
}
document.addEventListener("keydown", (event) => {
  const way = { ArrowRight: "[data-next]", ArrowLeft: "[data-back]" }[event.key];
  const there = way && !event.altKey && !event.ctrlKey && !event.metaKey && document.querySelector(way);
  if (there) there.click();
});
