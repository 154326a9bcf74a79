// As if a person looked: a build then names its stages, and a trial knows where it was.
process.stdout.isTTY = true
delete process.env.CI
