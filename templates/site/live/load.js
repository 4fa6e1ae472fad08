// Data of cards, by classic script tags, so that it works from a folder too. A data script calls Data.put.
const Data = (() => {
  "use strict"

  const root = document.documentElement.dataset.root || ""
  const there = {}
  const asked = {}

  function script(path) {
    asked[path] = asked[path] || new Promise((done, failed) => {
      const tag = h("script", { src: root + path, onload: done, onerror: () => failed(new Error(`${path} is not there`)) })
      document.head.append(tag)
    })
    return asked[path]
  }

  const put = (name, content) => { there[name] = content }

  async function get(name) {
    if (!(name in there)) await script(`data/${name}.js`)
    return there[name]
  }

  // By id a card's data, and what it needs of all the cards that have a say in it.
  async function card(family, id) {
    const { shared, cards } = await get(`${family}/${id}`)
    for (const one of Object.values(cards)) Object.assign(one, shared)
    return cards
  }

  // The modules that pages seldom need.
  const seldom = () => script(document.documentElement.dataset.seldom)

  return { put, get, card, seldom, root }
})()
