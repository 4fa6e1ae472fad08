// A job as the file that procgen takes, and back. Written in block style with every text in quotes; only that is read.
const JobFile = (() => {
  "use strict"

  const PLAIN = /^[A-Za-z][A-Za-z0-9_-]*$/
  const WORDS = ["true", "false", "null", "yes", "no", "on", "off", "y", "n"]
  const KEYS = ["id", "title", "family", "variant", "build"]
  const OF_SESSION = ["id", "card", "on", "by", "temperature", "gauge", "continues"]

  const scalar = text => PLAIN.test(text) && !WORDS.includes(String(text).toLowerCase()) ? text : JSON.stringify(String(text))
  const isThere = value => value !== null && value !== undefined && value !== "" &&
    !(typeof value === "object" && !Object.values(value).some(isThere))

  function* lines(content, indent, inOrder) {
    const pad = " ".repeat(indent)
    for (const key of inOrder ? inOrder(content) : Object.keys(content)) {
      const value = content[key]
      if (!isThere(value)) continue
      if (Array.isArray(value)) {
        yield `${pad}${scalar(key)}:`
        for (const item of value) {
          if (typeof item !== "object") {
            yield `${pad}  - ${scalar(item)}`
            continue
          }
          const [first, ...rest] = lines(item, indent + 4)
          yield `${pad}  - ${first.trimStart()}`
          yield* rest
        }
      } else if (typeof value === "object") {
        yield `${pad}${scalar(key)}:`
        yield* lines(value, indent + 2, depths)
      } else yield `${pad}${scalar(key)}: ${key === "count" ? value : scalar(value)}`
    }
  }

  // Depths in order of depth: an object would have whole numbers first.
  function depths(content) {
    const keys = Object.keys(content)
    return keys.every(key => /^[\d.]+$/.test(key)) ? keys.sort((a, b) => parseFloat(a) - parseFloat(b)) : keys
  }

  function write(job) {
    const known = Object.fromEntries(KEYS.map(key => [key, job[key]]))
    const sessions = job.sessions.filter(one => isThere(one.readings)).map(({ readings, ...session }) => ({ ...session, ...readings }))
    const content = { format: "job/1", ...known, marks: job.marks, gauges: job.gauges, shelf: job.shelf, sessions, overrides: job.overrides }
    return [...lines(content, 0)].join("\n").replace("format: \"job/1\"", "format: job/1") + "\n"
  }

  class NotOurs extends Error {}

  function wrong(number, what) {
    return new NotOurs(`Line ${number}: ${what}. This page reads the job files that it wrote itself; procgen job reads all others.`)
  }

  // The lines of a file as [number, indent, isItem, key, value]; an item's first key counts as indented past the dash.
  function split(text) {
    const found = []
    text.split(/\r?\n/).forEach((line, index) => {
      if (!line.trim() || /^\s*#/.test(line)) return
      const alone = /^( *)- ("(?:[^"\\]|\\.)*"|[A-Za-z0-9_.-]+)$/.exec(line)
      if (alone) return found.push([index + 1, alone[1].length + 2, true, null, alone[2]])
      const match = /^( *)(- )?("(?:[^"\\]|\\.)*"|[A-Za-z0-9_.-]+):(?: (.*))?$/.exec(line)
      if (!match) throw wrong(index + 1, `“${line.trim()}” is not of the form that it writes`)
      const [, pad, dash = "", key, value = ""] = match
      found.push([index + 1, pad.length + dash.length, dash !== "", unquoted(key, index + 1), value.trim()])
    })
    return found
  }

  function unquoted(text, number) {
    if (text[0] === "\"") {
      try {
        return JSON.parse(text)
      } catch {
        throw wrong(number, `${text} is not closed`)
      }
    }
    if (!/^[A-Za-z0-9_./-]+$/.test(text)) throw wrong(number, `“${text}” stands without quotes`)
    return text
  }

  function parse(text) {
    const all = split(text)
    let at = 0

    function map(indent) {
      const content = {}
      for (let first = true; at < all.length; first = false) {
        const [number, depth, isItem, key, value] = all[at]
        if (depth < indent || (isItem && !first)) break
        if (depth > indent || key === null) throw wrong(number, "it is indented otherwise")
        if (Object.hasOwn(content, key) || key === "__proto__") throw wrong(number, `“${key}” stands there twice`)
        at += 1
        content[key] = value ? unquoted(value, number) : below(indent)
      }
      return content
    }

    function below(indent) {
      if (at >= all.length || all[at][1] <= indent) return null
      if (!all[at][2]) return map(all[at][1])
      const items = []
      const depth = all[at][1]
      while (at < all.length && all[at][2] && all[at][1] === depth) {
        const [number, , , key, value] = all[at]
        if (key === null) at += 1
        items.push(key === null ? unquoted(value, number) : map(depth))
      }
      return items
    }

    const content = map(0)
    if (at < all.length) throw wrong(all[at][0], "it is indented otherwise")
    return content
  }

  function read(text) {
    const { format, sessions, overrides, ...rest } = parse(text)
    if (format !== "job/1") throw new NotOurs("This is no job file: it does not begin with “format: job/1”.")
    const strange = Object.keys(rest).find(key => ![...KEYS, "marks", "gauges", "shelf"].includes(key))
    if (strange) throw new NotOurs(`This page does not keep “${strange}” of a job; procgen job reads the file.`)
    if (!rest.id || !rest.family) throw new NotOurs("The job has no id, or does not say of which family it is.")
    return {
      variant: null, gauges: {}, ...rest, overrides: overrides || [],
      sessions: (sessions || []).map(session => {
        const own = Object.entries(session)
        const of = pick => Object.fromEntries(own.filter(([key]) => OF_SESSION.includes(key) === pick))
        return { ...of(true), readings: of(false) }
      }),
    }
  }

  return { write, read, NotOurs }
})()
