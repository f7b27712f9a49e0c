/* The page's own script: sends forms without leaving the page, puts pushed parts in place, keeps focus and scrolling.
   Without it every form still works as a form. */
"use strict";
(() => {
  const body = document.body;
  const status = document.getElementById("status");
  const say = (words) => { if (status.textContent !== words) status.textContent = words; };

  /* What is being typed, and what is folded, stays; everything else becomes what the server says. */
  const keep = () => ({
    morphStyle: "innerHTML",
    ignoreActiveValue: !!document.activeElement?.matches("input, select"),
    restoreFocus: true,
    callbacks: { beforeAttributeUpdated: (name, node) => !(name === "open" && node.tagName === "DETAILS") },
  });

  const toEnd = (log) => { log.scrollTop = log.scrollHeight; };
  const newest = (part) => { const all = part.querySelectorAll(".log li.entry"); return all.length ? all[all.length - 1].id : ""; };

  function place(name, html) {
    const part = document.getElementById("part-" + name);
    if (!part) return;
    const log = part.querySelector(".log");
    const atEnd = log && log.scrollHeight - log.scrollTop - log.clientHeight < 80;
    const before = newest(part);
    const hadFocus = part.contains(document.activeElement);
    Idiomorph.morph(part, html, keep());
    const after = newest(part);
    const now = part.querySelector(".log");
    if (now && (atEnd || before !== after)) toEnd(now);
    if (hadFocus && !part.contains(document.activeElement)) (now || part.querySelector("button, a"))?.focus({ preventScroll: true });
    if (before !== after) markFresh(name);
  }

  /* --- one phone at a time: a mark on what has news */
  const views = [...document.querySelectorAll(".views input")];
  function markFresh(name) {
    const view = views.find((one) => one.value === name);
    if (view && !view.checked) view.nextElementSibling.classList.add("fresh");
  }
  views.forEach((view) => view.addEventListener("change", () => {
    view.nextElementSibling.classList.remove("fresh");
    document.querySelectorAll(".log").forEach(toEnd);
    try { sessionStorage.setItem("view", view.value); } catch { /* without storage the first view is shown */ }
  }));
  try {
    const kept = views.find((one) => one.value === sessionStorage.getItem("view"));
    if (kept) kept.checked = true;
  } catch { /* as above */ }

  /* --- sending */
  async function send(form, button) {
    const data = new FormData(form, button);
    const isFile = form.enctype === "multipart/form-data";
    form.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(form.action, {
        method: "POST", headers: { "x-page": "script" }, body: isFile ? data : new URLSearchParams(data),
      });
      if (answer.ok) say("");
      else say(answer.status === 403 ? "The trial was started anew: open the address it printed." : await answer.text());
      if (answer.ok && form.hasAttribute("data-clears")) form.reset();
    } catch {
      say("The trial does not answer. Was it stopped?");
    } finally {
      form.removeAttribute("aria-busy");
    }
  }
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.hasAttribute("data-act")) return;
    event.preventDefault();
    send(form, event.submitter);
    /* a choice is made once: what stands in its place next must not get a second key press */
    if (form.classList.contains("choices")) form.closest(".log").focus({ preventScroll: true });
  });
  document.addEventListener("change", (event) => {
    const field = event.target;
    if (field.matches("[data-sends]") || (field.type === "file" && field.files.length)) field.form.requestSubmit();
  });

  /* --- the plan editor: read again while it is typed */
  const editor = document.getElementById("editor");
  let waiting = 0;
  let touched = false;
  let asked = 0;
  async function preview(fresh) {
    const turn = ++asked;
    const typed = fresh ? "" : new URLSearchParams(new FormData(editor));
    const answer = await fetch(editor.dataset.preview, { method: "POST", body: typed,
      headers: { "content-type": "application/x-www-form-urlencoded" } }).catch(() => null);
    if (answer && answer.ok && turn === asked) {
      Idiomorph.morph(document.getElementById("part-editor"), await answer.text(), keep());
    }
  }
  editor.addEventListener("input", () => { touched = true; clearTimeout(waiting); waiting = setTimeout(preview, 200); });
  editor.addEventListener("submit", () => { touched = false; });

  /* --- what the program pushes */
  let version = document.querySelector("[data-version]")?.dataset.version;
  const stream = new EventSource(`/events?p=${encodeURIComponent(body.dataset.patient)}&many=${body.dataset.many}`);
  stream.addEventListener("part", (event) => {
    const { name, html } = JSON.parse(event.data);
    place(name, html);
    if (name === "plan") {
      const found = document.querySelector("[data-version]")?.dataset.version;
      if (found !== version && !touched) preview(true);
      version = found;
    }
  });
  stream.addEventListener("still", () => { body.dataset.live = "yes"; });
  stream.addEventListener("open", () => { if (body.dataset.live === "lost") say(""); });
  stream.addEventListener("error", () => {
    if (body.dataset.live) say("The trial does not answer. Was it stopped?");
    body.dataset.live = "lost";
  });

  /* a picture gets its height late: what stood at the end stays at the end */
  document.addEventListener("load", (event) => {
    const log = event.target.closest?.(".log");
    if (log && log.scrollHeight - log.scrollTop - log.clientHeight < event.target.offsetHeight + 120) toEnd(log);
  }, true);
  document.querySelectorAll(".log").forEach(toEnd);
})();
