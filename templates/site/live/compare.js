// The page that sets one card of two families side by side: compare.html#card=…&a=…&b=…
const Compare = (() => {
  "use strict"

  async function make(place) {
    const index = await Data.get("search")
    const families = new Map(index.cards.map(([name, , path]) => [path.split("/")[0], name]))
    const cards = new Map(index.cards.map(([, title, path]) => [path.split("/")[1], title]))
    const asked = new URLSearchParams(location.hash.slice(1))
    const choice = (words, from, name, otherwise) => {
      const list = h("select", { name, onchange: show }, [...from].map(([id, title]) => h("option", { value: id }, title)))
      list.value = from.has(asked.get(name)) ? asked.get(name) : otherwise
      return [h("label", {}, `${words} `, list), list]
    }
    const [first, second] = [...families.keys()]
    const lists = [choice("Card", cards, "card", [...cards.keys()][0]), choice("of", families, "a", first), choice("beside", families, "b", second || first)]
    const said = h("div", { "aria-live": "polite" })
    place.replaceChildren(h("p", { class: "choices" }, lists.map(([label]) => label)), said)

    async function show() {
      const [card, a, b] = lists.map(([, list]) => list.value)
      history.replaceState(null, "", `#${new URLSearchParams({ card, a, b })}`)
      const [one, other] = await Promise.all([a, b].map(family => Data.get(`${family}/${card}.said`)))
      said.replaceChildren(Differences.make(one.items, other.items, families.get(a), families.get(b)))
    }
    await show()
  }

  return { make }
})()
