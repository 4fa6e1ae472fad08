// How two cards differ, in the words of `procgen compare`: each thing that is not the same, and what the one and the other
// say of it. A card comes as its items, in reading order: [kind, name, what it is called, what it says].
const Differences = (() => {
  "use strict"

  const NOTHING = null // what the other card has nothing like
  const ALIKE = 0.55 // from here on two texts are one that was reworded, as in procgen/ledger/changes.py
  const CALLED_BY_TEXT = ["step", "caution"]
  const ONCE = ["family", "title", "stage", "reason", "bring", "record", "hold"]

  // The places of `a` and of `b` that are not in their longest run of items in common.
  function apart(a, b) {
    const long = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1))
    for (let i = a.length - 1; i >= 0; i -= 1) {
      for (let j = b.length - 1; j >= 0; j -= 1) {
        long[i][j] = a[i] === b[j] ? long[i + 1][j + 1] + 1 : Math.max(long[i + 1][j], long[i][j + 1])
      }
    }
    const [gone, come] = [[], []]
    for (let i = 0, j = 0; i < a.length || j < b.length;) {
      if (i < a.length && j < b.length && a[i] === b[j]) [i, j] = [i + 1, j + 1]
      else if (j >= b.length || (i < a.length && long[i + 1][j] >= long[i][j + 1])) gone.push(i++)
      else come.push(j++)
    }
    return [gone, come]
  }

  // Of 1: the share of words that two texts have in common.
  function likeness(one, other) {
    const [ours, theirs] = [one, other].map(text => text.split(/\s+/))
    const rest = [...theirs]
    const shared = ours.filter(word => rest.includes(word) && rest.splice(rest.indexOf(word), 1)).length
    return (2 * shared) / (ours.length + theirs.length)
  }

  // Its counterpart: the very same in another place, that of its name, or what reads most like it.
  function counterpart([kind, name, head, text], among) {
    const same = among.filter(other => other[0] === kind)
    const equal = same.find(other => other[1] === name && other[3] === text)
    if (equal || ONCE.includes(kind)) return equal || same[0]
    if (name && kind !== "caution") return same.find(other => other[1] === name) || same.find(other => other[2] === head)
    const rated = same.map(other => [likeness(other[3], text), other]).sort(([x], [y]) => y - x)
    return rated.length && rated[0][0] >= ALIKE ? rated[0][1] : undefined
  }

  const bare = ([kind, , head]) => CALLED_BY_TEXT.includes(kind) ? head.split(" “")[0] : head
  const said = one => one[0] === "drawing" ? one[1] : one[3] || one[1]

  // What is not the same of two counterparts: of many lines those alone.
  function pair(ours, theirs) {
    if (ours[0] === "drawing" || ours[3] === theirs[3]) return [theirs[2], "", ""]
    const [a, b] = [ours, theirs].map(one => one[3].split("\n"))
    const [left, right] = [a.filter(line => !b.includes(line)), b.filter(line => !a.includes(line))]
    return [ours[2] === theirs[2] ? theirs[2] : bare(theirs), left.join("\n"), right.join("\n")]
  }

  // [what, what the one says, what the other says] each; both empty where only the eye sees it.
  function all(a, b) {
    const [gone, come] = apart(...[a, b].map(items => items.map(item => JSON.stringify(item))))
    const left = gone.map(at => a[at])
    const found = []
    for (const theirs of come.map(at => b[at])) {
      const ours = counterpart(theirs, left)
      if (ours) left.splice(left.indexOf(ours), 1)
      found.push(ours ? pair(ours, theirs) : [bare(theirs), NOTHING, said(theirs)])
    }
    return [...found, ...left.map(ours => [bare(ours), said(ours), NOTHING])]
  }

  // What differs alike stands together.
  function together(found) {
    const alike = new Map()
    for (const [what, one, other] of found) {
      const key = JSON.stringify([one, other])
      alike.set(key, [...(alike.get(key) || []), what])
    }
    return [...alike].map(([key, whats]) => [[...new Set(whats)].join("; "), ...JSON.parse(key)])
  }

  function make(a, b, first, second) {
    const found = together(all(a, b))
    if (!found.length) return h("p", {}, "The two say the same.")
    const side = (words, text) => h("div", {}, h("dt", {}, words),
      (text || "–").split("\n").map(line => h("dd", {}, line.replace(" -> ", " → "))))
    const called = (what, one, other) => one === NOTHING ? `${what}, ${second} only` : other === NOTHING ? `${what}, ${first} only`
      : one || other ? what : `${what}: not the same`
    return h("ol", { class: "differences" }, found.map(([what, one, other]) => h("li", {},
      h("p", { class: "at" }, called(what, one, other)),
      (one || other) && h("dl", {}, one !== NOTHING && side(first, one), other !== NOTHING && side(second, other)))))
  }

  return { make, all }
})()
