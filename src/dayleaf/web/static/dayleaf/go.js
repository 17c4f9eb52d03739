// What a child's page cannot say in HTML: digits to touch, and the device's own voice. Both stay hidden without it.
const field = document.querySelector("#answer");
const pad = document.querySelector(".pad");
if (field && pad) {
  pad.hidden = false;
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("button");
    if (!key) return;
    if ("back" in key.dataset) field.value = field.value.slice(0, -1);
    else if (field.value.length < field.maxLength) field.value += key.dataset.digit;
  });
}
const aloud = document.querySelector(".aloud");
if (aloud && "speechSynthesis" in window) {
  aloud.hidden = false;
  aloud.addEventListener("click", () => {
    const words = new SpeechSynthesisUtterance(aloud.dataset.say);
    words.lang = aloud.dataset.lang || "en";
    words.rate = 0.85;
    window.speechSynthesis.cancel();
    window.speechSynthesis.speak(words);
  });
}
