// A job as the file that procgen takes, and back. Written in block style with every text in quotes; read as people write it:
// in blocks or braces, with or without quotes and comments.
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
    return new NotOurs(`Line ${number}: ${what}. Nothing was read; procgen job says more of a file.`)
  }

  // What stands before a comment: a # behind a space, outside of quotes. Quotes open where a value may begin.
  function uncommented(line) {
    let quote = null
    for (let i = 0; i < line.length; i += 1) {
      const sign = line[i]
      if (quote) {
        if (sign === "\\" && quote === "\"") i += 1
        else if (sign === quote) quote = null
      } else if (/["']/.test(sign) && /(^|[[{,:-]\s*|\s)$/.test(line.slice(0, i))) quote = sign
      else if (sign === "#" && /(^|\s)$/.test(line.slice(0, i))) return line.slice(0, i).trimEnd()
    }
    return line.trimEnd()
  }

  // One value that begins in a line and may go on in those below: { }, [ ], quotes, or plain words.
  class Flow {
    constructor(text, number, more) {
      Object.assign(this, { text, number, more, at: 0 })
    }

    // The next sign that is no space, fetched from the next line where this one is done.
    peek() {
      while (/\s/.test(this.text[this.at] || "")) this.at += 1
      if (this.at < this.text.length) return this.text[this.at]
      const more = this.more()
      if (more === null) throw wrong(this.number, "a bracket is not closed")
      this.text += ` ${more}`
      return this.peek()
    }

    take(pattern) {
      const found = new RegExp(pattern, "y")
      found.lastIndex = this.at
      const [all] = found.exec(this.text) || [""]
      this.at += all.length
      return all
    }

    value(inside) {
      const sign = this.peek()
      if (sign === "{") return this.map()
      if (sign === "[") return this.list()
      if (sign === "\"" || sign === "'") return this.quoted()
      return plain(inside ? this.words() : this.take(".*").trim(), this.number)
    }

    // Plain words inside brackets, which may go on in the next line.
    words() {
      const said = []
      for (let more = true; more; more = said[said.length - 1] !== "" && !/[,\[\]{}:]/.test(this.peek())) {
        said.push(this.take("(?:[^,\\[\\]{}:]|:(?=[^\\s,\\[\\]{}]))*").trim())
      }
      return said.join(" ").trim()
    }

    quoted() {
      const found = this.take(this.text[this.at] === "'" ? "'(?:[^']|'')*'" : "\"(?:[^\"\\\\]|\\\\.)*\"")
      if (!found) throw wrong(this.number, "a quote is not closed in its line")
      if (found[0] === "'") return found.slice(1, -1).replaceAll("''", "'")
      try {
        return JSON.parse(found)
      } catch {
        throw wrong(this.number, `${found} has a backslash that means nothing here`)
      }
    }

    list() {
      const items = []
      for (this.at += 1; this.peek() !== "]"; this.next("]")) items.push(this.value(true))
      this.at += 1
      return items
    }

    map() {
      const content = {}
      for (this.at += 1; this.peek() !== "}"; this.next("}")) {
        const key = this.value(true)
        if (this.peek() !== ":") throw wrong(this.number, `“${key}” has no value`)
        this.at += 1
        set(content, key, /[,}]/.test(this.peek()) ? null : this.value(true), this.number)
      }
      this.at += 1
      return content
    }

    next(end) {
      const sign = this.peek()
      if (sign === ",") this.at += 1
      else if (sign !== end) throw wrong(this.number, `a comma or ${end} is missing`)
    }
  }

  function plain(text, number) {
    if (["", "~", "null"].includes(text)) return null
    if (/^[&*!|>%@`]/.test(text)) throw wrong(number, `“${text}” begins with a sign that this page does not read`)
    if (/:(\s|$)/.test(text)) throw wrong(number, `“${text}” has a second colon; put quotes round it`)
    return text
  }

  function set(content, key, value, number) {
    if (typeof key !== "string") throw wrong(number, "a key is missing before the colon")
    if (Object.hasOwn(content, key) || key === "__proto__") throw wrong(number, `“${key}” stands there twice`)
    content[key] = value
  }

  const KEY = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|[^\s"'{[#][^#]*?):(?=\s|$)\s*/

  function parse(text) {
    // [number, indent, what stands there] of each line that says something.
    const written = text.replace(/^\uFEFF/, "").split(/\r?\n/)
    const rows = written.map((line, index) => [index + 1, line.search(/\S|$/), uncommented(line).trim()]).filter(([, , said]) => said)
    let at = 0
    const isItem = () => /^-(\s|$)/.test(rows[at][2])
    const isAt = indent => at < rows.length && rows[at][1] === indent

    function inline(said, number, indent) {
      const head = /^([|>])([-+]?)([1-9]?)([-+]?)$/.exec(said)
      if (head) return texts(number, indent, head[1] === ">", head[2] || head[4], head[3])
      const flow = new Flow(said, number, () => at < rows.length ? rows[at++][2] : null)
      const value = flow.value(false)
      if (flow.text.slice(flow.at).trim()) throw wrong(number, `“${flow.text.slice(flow.at).trim()}” stands after the value`)
      return typeof value === "string" && !/^["'[{]/.test(said) ? goneOn(value, indent) : value
    }

    // The text below | or >, as it stands: what is set in further than `indent`, or by `more`.
    function texts(number, indent, isFolded, end, more) {
      const into = line => line.search(/[^ ]/)
      let last = number
      while (last < written.length && !(into(written[last]) >= 0 && into(written[last]) <= indent)) last += 1
      while (at < rows.length && rows[at][0] <= last) at += 1
      const own = written.slice(number, last)
      const first = own.find(line => into(line) >= 0)
      const inset = more ? indent + Number(more) : first ? into(first) : Infinity
      const odd = own.findIndex(line => into(line) >= 0 && into(line) < inset)
      if (odd >= 0) throw wrong(number + odd + 1, "it is indented otherwise")
      const all = own.map(line => `${line.slice(inset)}\n`).join("").slice(0, last < written.length ? undefined : -1)
      const text = end === "+" ? all : all.replace(/\n+$/, end || !all.trim() ? "" : "\n")
      return isFolded ? text.replace(/^([^ \t\n].*)\n(\n*)(?=[^ \t\n])/gm, (_, line, gap) => line + (gap || " ")) : text
    }

    // Plain words go on in lines that are set in further.
    function goneOn(value, indent) {
      while (at < rows.length && rows[at][1] > indent) {
        if (KEY.test(rows[at][2]) || isItem()) throw wrong(rows[at][0], "it is indented otherwise")
        value += ` ${rows[at++][2]}`
      }
      return value
    }

    function below(indent, orItems) {
      if (at < rows.length && rows[at][1] > indent) return block(rows[at][1])
      return orItems && isAt(indent) && isItem() ? block(indent) : null
    }

    function block(indent) {
      return isItem() ? list(indent) : map(indent)
    }

    function list(indent) {
      const items = []
      while (isAt(indent) && isItem()) {
        const [number, , said] = rows[at]
        const rest = said.slice(1).trim()
        if (!KEY.test(rest)) {
          at += 1
          items.push(rest ? inline(rest, number, indent) : below(indent))
          continue
        }
        const inner = indent + said.length - rest.length
        rows[at] = [number, inner, rest]
        items.push(map(inner))
      }
      return items
    }

    function map(indent) {
      const content = {}
      while (isAt(indent) && !isItem()) {
        const [number, , said] = rows[at++]
        const [all, key] = KEY.exec(said) || []
        if (!all) throw wrong(number, `“${said}” is no key with its value`)
        const rest = said.slice(all.length)
        set(content, new Flow(key, number, () => null).value(false), rest ? inline(rest, number, indent) : below(indent, true), number)
      }
      if (at < rows.length && rows[at][1] > indent) throw wrong(rows[at][0], "it is indented otherwise")
      return content
    }

    const whole = rows.length > 0 && rows[0][2].startsWith("{")  // JSON is YAML too
    const content = whole ? inline(rows[at++][2], rows[0][0], 0) : rows.length ? map(rows[0][1]) : {}
    if (at < rows.length) throw wrong(rows[at][0], "it is indented otherwise")
    return content
  }

  // In what a bare figure is read here.
  const USUAL = { length: ["mm"], mass: ["kg"], angle: ["deg", "°"], temperature: ["°C"] }

  function read(text) {
    const { format, units, sessions, overrides, ...rest } = parse(text)
    if (format !== "job/1") throw new NotOurs("This is no job file: it does not begin with “format: job/1”.")
    const other = Object.entries(units || {}).find(([of, unit]) => unit !== null && !(USUAL[of] || []).includes(unit))
    if (other) {
      throw new NotOurs(`Bare figures of this file are in ${other[1]}, and on this page in mm, kg, ° and °C. Write the unit behind each
        figure and leave “units” out; or give the file to procgen job.`.replace(/\s+/g, " "))
    }
    const strange = Object.keys(rest).find(key => ![...KEYS, "marks", "gauges", "shelf"].includes(key))
    if (strange) throw new NotOurs(`This page does not keep “${strange}” of a job; procgen job reads the file.`)
    if ([sessions || [], overrides || []].some(one => !Array.isArray(one) || one.some(it => it === null || typeof it !== "object"))) {
      throw new NotOurs("Sessions and overrides are lists of entries, each begun by a dash; these are not.")
    }
    if (!rest.id || !rest.family) throw new NotOurs("The job has no id, or does not say of which family it is.")
    return {
      ...rest, variant: rest.variant ?? null, gauges: rest.gauges || {}, overrides: overrides || [],
      sessions: (sessions || []).map(session => {
        const own = Object.entries(session)
        const of = pick => Object.fromEntries(own.filter(([key]) => OF_SESSION.includes(key) === pick))
        return { ...of(true), readings: of(false) }
      }),
    }
  }

  return { write, read, NotOurs }
})()
