// The few things that a page cannot say in HTML: which time zone this is, and a printed page's own window.
document.querySelectorAll("input[data-time-zone]").forEach((field) => {
  field.value = Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC";
});

// After today's pages were opened, the day is read again, so that it says what was printed.
document.addEventListener("visibilitychange", () => {
  const stale = document.querySelector("form.print[data-opened]");
  if (document.visibilityState === "visible" && stale) window.location.reload();
});
document.addEventListener("submit", (event) => {
  if (!event.target.matches("form[target]")) return;
  if (event.target.closest("article")) event.target.dataset.opened = "yes";
  const busy = Object.assign(document.createElement("p"), { className: "busy", textContent: document.body.dataset.setting });
  busy.setAttribute("role", "status");
  event.target.querySelectorAll(".busy").forEach((old) => old.remove());
  event.target.append(busy);
  setTimeout(() => busy.remove(), 8000);
});

// A photo is made small enough for reading before it is sent: that is quicker, and what it tells of its place stays behind.
const LONGEST = 2400;
async function smaller(file) {
  const picture = await createImageBitmap(file);
  const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const canvas = Object.assign(document.createElement("canvas"), {
    width: Math.round(picture.width * scale),
    height: Math.round(picture.height * scale),
  });
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.9));
  return new File([blob], file.name, { type: "image/jpeg" });
}
document.querySelectorAll("input[data-shrink]").forEach((field) => {
  field.addEventListener("change", async () => {
    const chosen = new DataTransfer();
    for (const file of field.files) {
      const photo = file.type.startsWith("image/") && file.size > 400000;
      chosen.items.add(photo ? await smaller(file).catch(() => file) : file);
    }
    field.files = chosen.files;
    field.form.requestSubmit();
  });
});
