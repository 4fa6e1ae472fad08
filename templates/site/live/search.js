// Search over titles, steps, cautions, plugs and values, as one types. The index is fetched when the box is entered:
// { cards: [[family, title, path], ...], lines: [[kind, text, [card, ...], anchors], ...] }.
const Search = (() => {
  "use strict"

  const MOST = 30
  const LINKS = 8 // of one line
  const plain = text => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/[^\p{L}\p{N}.]+/gu, " ")
  let ready = null

  function prepare(index) {
    const texts = index.lines.map(([, text]) => ` ${plain(text)}`)
    return { ...index, texts }
  }

  // The lines that have all the words, each at the beginning of a word; titles before steps, then as the cards go.
  function find(index, typed) {
    const words = plain(typed).split(" ").filter(word => word).map(word => ` ${word}`)
    if (!words.length) return []
    const found = []
    for (let place = 0; place < index.texts.length; place += 1) {
      if (words.every(word => index.texts[place].includes(word))) found.push(place)
    }
    return found
  }

  function make(family) {
    const box = h("input", { type: "search", autocomplete: "off", placeholder: "find step, plug, value", "aria-label": "Find a step, a plug, a value", "aria-controls": "found" })
    const count = h("p", { role: "status", class: "said" })
    const list = h("ul", { id: "found", class: "found" })
    const show = () => {
      const all = ready ? find(ready, box.value) : []
      const isOwn = place => ready.lines[place][2].some(card => ready.cards[card][2].startsWith(`${family}/`))
      const found = family ? [...all.filter(isOwn), ...all.filter(place => !isOwn(place))] : all
      const typed = box.value.trim()
      const shown = found.length > MOST ? `, the first ${MOST} shown` : ""
      count.textContent = typed && ready ? `${found.length} found${shown}` : ""
      list.replaceChildren(...found.slice(0, MOST).map(place => entry(ready, place, family)))
    }
    box.addEventListener("focus", async () => {
      ready = ready || prepare(await Data.get("search"))
      show()
    })
    box.addEventListener("input", show)
    box.addEventListener("keydown", event => {
      if (event.key === "Escape") {
        box.value = ""
        show()
      }
    })
    return h("search", { onkeydown: event => { if (event.key === "Escape") box.focus() } }, h("span", { class: "enter cut text" }, box), count, list)
  }

  // A line once, with a link for each card that says it; of the family that one is in, only that.
  function entry(index, place, family) {
    const [kind, text, cards, anchor] = index.lines[place]
    const own = cards.filter(card => index.cards[card][2].startsWith(`${family}/`))
    const links = (own.length ? own : cards).map((card, place) => {
      if (place >= LINKS) return ""
      const [name, title, path] = index.cards[card]
      return h("a", { href: `${Data.root}${path}.html${anchor && "#"}${anchor}` }, kind === "card" ? name : `${name}: ${title}`)
    })
    const more = links.length > LINKS ? ` and ${links.length - LINKS} more` : ""
    return h("li", {}, h("p", {}, kind !== "step" && kind !== "card" && h("span", { class: "kind" }, `${kind} `), text),
      h("p", { class: "links" }, links.slice(0, LINKS).flatMap((link, n) => n ? [" ", link] : [link]), more))
  }

  return { make, find, prepare }
})()
