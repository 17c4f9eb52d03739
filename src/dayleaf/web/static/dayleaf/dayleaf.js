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
  if (event.target.matches("form.print")) event.target.dataset.opened = "yes";
});
