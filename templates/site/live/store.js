// What this device keeps: jobs, ticks and counts of each job, settings. Nothing of it leaves the device by itself.
const Store = (() => {
  "use strict"

  // Several shops' sites may share one origin, and all files of a folder do.
  const prefix = `cards/${document.documentElement.dataset.shop || ""}/`
  let memory = {} // where the browser keeps nothing

  function get(name, otherwise) {
    try {
      const text = localStorage.getItem(prefix + name)
      return text === null ? otherwise : JSON.parse(text)
    } catch {
      return name in memory ? memory[name] : otherwise
    }
  }

  function set(name, value) {
    try {
      localStorage.setItem(prefix + name, JSON.stringify(value))
    } catch {
      memory[name] = value
    }
  }

  const jobs = family => Object.values(get("jobs", {})).filter(job => !family || job.family === family)
  const job = id => get("jobs", {})[id] || null

  function saveJob(one) {
    set("jobs", { ...get("jobs", {}), [one.id]: one })
  }

  // The job that is worked on, of a family.
  const current = family => job(get(`current/${family}`, ""))
  const setCurrent = (family, id) => set(`current/${family}`, id)

  // Of a job and card: steps ticked, members counted by reading, the day it was done.
  const marks = (id, card) => ({ ticks: [], counted: {}, done: "", ...get(`marks/${id}/${card}`, {}) })
  const saveMarks = (id, card, what) => set(`marks/${id}/${card}`, what)

  // Which member was open, by axis: a phone forgets a page that it was turned away from, and A2's box looks like A1's.
  const open = (id, card) => get(`open/${id}/${card}`, {})
  const saveOpen = (id, card, members) => set(`open/${id}/${card}`, members)

  return { get, set, jobs, job, saveJob, current, setCurrent, marks, saveMarks, open, saveOpen }
})()
