// Follows the maker's saves: shapes at once, the rest when it is worked out; a mistake leaves the view.
"use strict";
(() => {
  const note = document.createElement("p");
  note.id = "note"; note.setAttribute("role", "alert"); note.hidden = true;
  document.body.prepend(note);
  const fetched = async (name) => (await fetch(`${name}?${Date.now()}`, { cache: "no-store" }));
  const put = async () => {
    await window.plan.load(await (await fetched("piece.glb")).arrayBuffer());
    document.querySelector("header").innerHTML = await (await fetched("head.html")).text();
    const opened = [...document.querySelectorAll("#rest details")].map((each) => each.open);
    document.getElementById("rest").innerHTML = await (await fetched("rest.html")).text();
    document.querySelectorAll("#rest details").forEach((each, i) => { each.open = Boolean(opened[i]); });
    window.plan.showTicks();
  };
  let last = Promise.resolve();
  const events = new EventSource("events");
  const changed = (event) => {
    note.hidden = true;
    last = last.then(put).then(() => {
      document.documentElement.dataset.shown = `${event.type} ${JSON.parse(event.data)}`;
    }).catch((error) => { note.hidden = false; note.textContent = String(error); });
  };
  events.addEventListener("piece", changed);
  events.addEventListener("rest", changed);
  events.addEventListener("mistake", (event) => { note.textContent = JSON.parse(event.data); note.hidden = false; });
  events.addEventListener("error", () => { note.textContent = "The script is not being watched any more."; note.hidden = false; });
  events.addEventListener("open", () => { note.hidden = true; });
})();
