// The job that is on the stand: chosen, begun, saved as a job file, read from one.
const JobPick = (() => {
  "use strict"

  const variants = data => Object.keys(data.variants).filter(id => id && !id.includes(">"))
  const idOf = title => title.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/[^a-z0-9]+/g, "-")
    .replace(/^[^a-z]+|-$/g, "") || "job"

  function free(id) {
    let made = id
    for (let count = 2; Store.job(made); count += 1) made = `${id}-${count}`
    return made
  }

  function make(desk) {
    const data = desk.cards[desk.id]
    const say = h("p", { role: "status", class: "said" })
    const tell = words => { say.textContent = words }
    const choose = h("select", { onchange: () => desk.use(Store.job(choose.value)) })
    const title = h("input", { type: "text", autocomplete: "off", maxlength: 60 })
    const variant = h("select", {}, variants(data).map(id => h("option", { value: id }, data.names[id] || id)))
    const begin = () => {
      if (!title.value.trim()) return title.focus()
      const job = { id: free(idOf(title.value)), title: title.value.trim(), family: desk.family,
        variant: variant.value || null, gauges: {}, sessions: [], overrides: [] }
      Store.saveJob(job)
      title.value = ""
      more.open = false
      desk.use(job)
      tell(`Readings of ${job.title} stay on this device. Save them as a job file to take them along.`)
    }
    const file = h("input", { type: "file", accept: ".yaml,.yml", class: "unseen", tabindex: -1, "aria-hidden": "true", onchange: async () => {
      if (file.files[0]) tell(await take(desk, await file.files[0].text()))
      file.value = ""
    } })
    const summary = h("summary", {})
    const more = h("details", { class: "begin" }, summary,
      h("p", {}, h("label", {}, "Name ", h("span", { class: "enter cut text" }, title))),
      variants(data).length > 1 && h("p", {}, h("label", {}, "Variant ", variant)),
      h("p", { class: "answers" }, h("button", { type: "button", onclick: begin }, "Begin this job"),
        h("button", { type: "button", onclick: () => file.click() }, "Read a job file"), file))
    const save = h("button", { type: "button", onclick: () => hand(desk.job) }, "Save as job file")
    const again = h("button", { type: "button", onclick: () => {
      desk.begin()
      desk.keep()
      tell("Another measuring is begun: what it reads takes the place of what was read before.")
    } }, "Measure anew")
    const own = h("p", { class: "answers" }, save, again)
    const which = h("p", {}, h("label", {}, "Readings for ", choose))
    desk.watch(() => {
      const jobs = Store.jobs(desk.family)
      choose.replaceChildren(h("option", { value: "" }, "none"), ...jobs.map(job => h("option", { value: job.id }, job.title || job.id)))
      choose.value = desk.job ? desk.job.id : ""
      own.hidden = !desk.job
      which.hidden = !jobs.length
      summary.textContent = jobs.length ? "Another job" : "Enter readings"
    })
    return h("section", { class: "job", "aria-label": "Job" }, which, own, more, say)
  }

  // What a job file's text comes to, in words.
  async function take(desk, text) {
    await Data.seldom()
    try {
      const job = JobFile.read(text)
      if (job.family !== desk.family) return `That job is a ${job.family}; this card is for a ${desk.family}.`
      const other = variants(desk.cards[desk.id])
      if (other.length && [job.variant, job.build || job.variant].some(one => !other.includes(one))) return `That job names no variant of this family: ${other.join(" or ")}.`
      const name = Store.job(job.id) ? free(job.id) : job.id
      Store.saveJob({ ...job, id: name })
      desk.use(Store.job(name))
      return name === job.id ? `${job.title || job.id} is read.` : `${job.title || job.id} is read as ${name}; ${job.id} was there already.`
    } catch (refused) {
      if (!(refused instanceof JobFile.NotOurs)) throw refused
      return refused.message
    }
  }

  async function hand(job) {
    await Data.seldom()
    const address = URL.createObjectURL(new Blob([JobFile.write(job)], { type: "text/yaml" }))
    h("a", { href: address, download: `${job.id}.yaml` }).click()
    setTimeout(() => URL.revokeObjectURL(address), 1000)
  }

  return { make, take }
})()
