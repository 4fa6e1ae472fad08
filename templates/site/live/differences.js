// How two cards differ, line by line: what only the one says and what only the other says, under the step it stands in.
const Differences = (() => {
  "use strict"

  // The longest lines in common, as [place in a, place in b] pairs.
  function common(a, b) {
    const long = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1))
    for (let i = a.length - 1; i >= 0; i -= 1) {
      for (let j = b.length - 1; j >= 0; j -= 1) {
        long[i][j] = a[i] === b[j] ? long[i + 1][j + 1] + 1 : Math.max(long[i + 1][j], long[i][j + 1])
      }
    }
    const pairs = []
    for (let i = 0, j = 0; i < a.length && j < b.length;) {
      if (a[i] === b[j]) pairs.push([i++, j++])
      else if (long[i + 1][j] >= long[i][j + 1]) i += 1
      else j += 1
    }
    return pairs
  }

  function blocks(a, b) {
    const found = []
    let [i, j] = [0, 0]
    for (const [x, y] of [...common(a, b), [a.length, b.length]]) {
      if (x > i || y > j) found.push([a.slice(i, x), b.slice(j, y), a.slice(0, x).reverse().find(line => /^\d/.test(line)) || ""])
      ;[i, j] = [x + 1, y + 1]
    }
    return found
  }

  function make(a, b, first, second) {
    const found = blocks(a, b)
    if (!found.length) return h("p", {}, "The two say the same.")
    const side = (words, lines) => lines.length
      ? [h("dt", {}, words), ...lines.map(line => h("dd", {}, line.trim()))] : []
    return h("ol", { class: "differences" }, found.map(([ours, theirs, step]) => h("li", {},
      step && !ours.includes(step) && h("p", { class: "at" }, step),
      h("dl", {}, side(`Only ${first}`, ours), side(`Only ${second}`, theirs)))))
  }

  return { make, blocks }
})()
