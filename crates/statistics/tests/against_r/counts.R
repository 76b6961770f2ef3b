# Rscript counts.R TABLE.csv: generalised linear (mixed) models of every design, as JSON.
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))); source(file.path(here, "shared.R"))
needed("lme4", "MASS", "jsonlite"); suppressMessages({library(lme4); library(MASS)})

tight <- glmerControl(optimizer = "bobyqa", tolPwrss = 1e-10, optCtrl = list(rhoend = 1e-9, maxfun = 1e5),
  check.conv.singular = "ignore", check.conv.grad = "ignore", check.conv.hess = "ignore")
exact <- glm.control(1e-13, 200)
told <- function(d) {
  kind <- as.character(d$kind[1])
  fit <- suppressWarnings(tryCatch(switch(kind,
    poisson = glm(seen ~ treatment + offset(known), poisson, d, control = exact),
    binomial = glm(cbind(seen, of - seen) ~ treatment + offset(known), binomial, d, control = exact),
    shaped = glm.nb(seen ~ treatment + offset(known), d, control = exact),
    blocks = glmer(seen ~ treatment + offset(known) + (1 | block), d, poisson, control = tight),
    crossed = glmer(cbind(seen, of - seen) ~ treatment + offset(known) + (1 | block) + (1 | site), d, binomial, control = tight)),
    error = function(e) NULL))
  if (is.null(fit)) return(list(failed = TRUE))
  mixed <- inherits(fit, "merMod"); V <- suppressWarnings(vcov(fit))
  spreads <- if (mixed) as.data.frame(VarCorr(fit)) else NULL
  list(failed = FALSE, log_likelihood = as.numeric(logLik(fit)),
    fixed = plain(if (mixed) fixef(fit) else coef(fit)), errors = plain(sqrt(diag(as.matrix(V)))),
    spreads = if (mixed) plain(setNames(spreads$sdcor, spreads$grp)[if (kind == "crossed") c("block", "site") else "block"]) else list(),
    shape = if (kind == "shaped") fit$theta else NULL, shape_error = if (kind == "shaped") fit$SE.theta else NULL,
    deviance = if (mixed) NULL else deviance(fit), pearson = if (mixed) NULL else sum(residuals(fit, "pearson")^2))
}
answer(lapply(designs(), told))
