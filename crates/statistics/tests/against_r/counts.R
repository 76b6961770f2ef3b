# Rscript counts.R TABLE.csv: generalised linear (mixed) models of every design, as JSON.
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))); source(file.path(here, "shared.R"))
needed("lme4", "MASS", "jsonlite"); suppressMessages({library(lme4); library(MASS)})

tight <- glmerControl(optimizer = "bobyqa", tolPwrss = 1e-10, optCtrl = list(rhoend = 1e-9, maxfun = 1e5),
  check.conv.singular = "ignore", check.conv.grad = "ignore", check.conv.hess = "ignore")
exact <- glm.control(1e-13, 200)
# Negative binomial counts in blocks at our own answer, by Laplace's approximation with the observed curvature, written out,
# and its slopes there: glmer takes the expected curvature, which is another approximation under the log link.
laplace <- function(d) {
  X <- model.matrix(~ treatment, d); blocks <- split(seq_along(d$seen), d$block); k <- ncol(X)
  ours <- as.numeric(strsplit(as.character(d$ours[1]), ";")[[1]])
  if (length(ours) != k + 2 || ours[k + 1] == 0) return(NULL)
  logs <- function(p) {
    place <- as.vector(X %*% p[1:k]) + d$known; sd <- exp(p[k + 1]); shape <- exp(p[k + 2])
    one <- function(rows) {
      y <- d$seen[rows]; u <- 0
      slopes <- function(u) { mu <- exp(place[rows] + u)
        c(sum(shape * (y - mu) / (shape + mu)) - u / sd^2, -sum(mu * shape * (shape + y) / (shape + mu)^2) - 1 / sd^2) }
      for (i in 1:30) { g <- slopes(u); u <- u - g[1] / g[2] }
      sum(dnbinom(y, size = shape, mu = exp(place[rows] + u), log = TRUE)) + dnorm(u, 0, sd, log = TRUE) +
        0.5 * log(2 * pi) - 0.5 * log(-slopes(u)[2])
    }
    sum(vapply(blocks, one, 0))
  }
  at <- c(ours[1:k], log(ours[k + 1]), log(ours[k + 2])); h <- 1e-4
  slope <- function(i) { step <- replace(numeric(k + 2), i, h); (logs(at + step) - logs(at - step)) / (2 * h) }
  structure(list(log_likelihood = logs(at), slopes = vapply(seq_len(k + 2), slope, 0)), class = "written_out")
}
told <- function(d) {
  kind <- as.character(d$kind[1])
  fit <- suppressWarnings(tryCatch(switch(kind,
    poisson = glm(seen ~ treatment + offset(known), poisson, d, control = exact),
    binomial = glm(cbind(seen, of - seen) ~ treatment + offset(known), binomial, d, control = exact),
    shaped = glm.nb(seen ~ treatment + offset(known), d, control = exact),
    blocks = glmer(seen ~ treatment + offset(known) + (1 | block), d, poisson, control = tight),
    shaped_blocks = laplace(d),
    crossed = glmer(cbind(seen, of - seen) ~ treatment + offset(known) + (1 | block) + (1 | site), d, binomial, control = tight)),
    error = function(e) NULL))
  if (is.null(fit)) return(list(failed = TRUE))
  if (inherits(fit, "written_out")) return(list(failed = FALSE, log_likelihood = fit$log_likelihood,
    slopes = plain(fit$slopes)))
  mixed <- inherits(fit, "merMod"); V <- suppressWarnings(vcov(fit))
  spreads <- if (mixed) as.data.frame(VarCorr(fit)) else NULL
  list(failed = FALSE, log_likelihood = as.numeric(logLik(fit)),
    fixed = plain(if (mixed) fixef(fit) else coef(fit)), errors = plain(sqrt(diag(as.matrix(V)))),
    spreads = if (mixed) plain(setNames(spreads$sdcor, spreads$grp)[if (kind == "crossed") c("block", "site") else "block"]) else list(),
    shape = if (kind == "shaped") fit$theta else NULL, shape_error = if (kind == "shaped") fit$SE.theta else NULL,
    deviance = if (mixed) NULL else deviance(fit), pearson = if (mixed) NULL else sum(residuals(fit, "pearson")^2))
}
answer(lapply(designs(), told))
