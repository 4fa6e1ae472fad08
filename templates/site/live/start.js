// Begins what a page has: units and search on each, the desk on a card, ticks of done cards on a deck.
(() => {
  "use strict"

  const root = document.documentElement.dataset

  async function card(place) {
    const { family, card: id } = place.dataset
    const head = place.querySelector(".start")
    Revision.show(place, head)
    if (!("live" in place.dataset)) return () => {}
    const cards = await Data.card(family, id).catch(() => null)
    if (!cards) {
      head.append(h("p", { class: "job", role: "status" }, "This device does not hold what judges readings here. Open this page once with a network."))
      return () => {}
    }
    const desk = new Desk(family, id, cards)
    head.append(JobPick.make(desk))
    desk.watch(() => place.toggleAttribute("data-job", Boolean(desk.job)))
    const steps = [...place.querySelectorAll(".steps > li")]
    for (const step of steps) {
      Ticks.step(desk, step)
      Entry.step(desk, step)
      Arms.values(desk, step)
      step.querySelectorAll(".arms[data-decision]").forEach(list => Arms.decision(desk, list))
    }
    place.querySelector(".foot").before(Ticks.done(desk, steps.map(step => step.id.replace(/^step-/, ""))))
    const bar = Bar.make(desk)
    place.append(bar)
    nearest(desk, steps)
    aside(bar)
    return () => desk.refresh()
  }

  // The decisions nearest below what one is entering.
  function nearest(desk, steps) {
    const decisions = steps.map(step => [...step.querySelectorAll(".arms[data-decision]")].map(list => list.dataset.decision))
    steps.forEach((step, place) => step.addEventListener("focusin", () => {
      const near = decisions.slice(place).find(names => names.length) || []
      if (String(near) === String(desk.near || [])) return
      desk.near = near
      desk.refresh()
    }))
  }

  // The verdict becomes part of the flow where a keypad leaves little room.
  function aside(bar) {
    const view = window.visualViewport
    if (!view) return
    const fit = () => bar.classList.toggle("aside", view.height < 400 || view.height < window.innerHeight * 0.75)
    view.addEventListener("resize", fit)
    fit()
  }

  // Boxes of a deck ticked for the cards that the job on the stand has done.
  function decks() {
    for (const link of document.querySelectorAll(".order a")) {
      const [family, id] = link.href.replace(/\.html$/, "").split("/").slice(-2)
      const job = Store.current(family)
      const done = job && Store.marks(job.id, id).done
      link.parentElement.classList.toggle("is-done", Boolean(done))
      if (done) link.append(h("span", { class: "unseen" }, ", done"))
    }
  }

  async function start() {
    let changed = () => {}
    const place = document.querySelector("article.card")
    const tools = h("header", { class: "tools" }, Search.make(place ? place.dataset.family : root.family || ""), Units.make(() => changed()))
    document.querySelector("#content").before(tools)
    decks()
    const compare = document.querySelector("[data-compare]")
    if (compare) {
      await Data.seldom()
      await Compare.make(compare)
    }
    if (place) changed = await card(place)
    document.documentElement.dataset.ready = "yes"
    if ("serviceWorker" in navigator && window.isSecureContext && location.protocol !== "file:") {
      navigator.serviceWorker.register(`${root.root || ""}sw.js`)
    }
  }

  start()
})()
