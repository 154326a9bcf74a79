/** What every page of the site runs: says that scripts run, so that styles may show what needs them. */
document.documentElement.classList.add('scripted')

export {}
