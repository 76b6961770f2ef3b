# Rscript ground.R TABLE.csv: neighbours that are alike along a row, and sites that scatter each by itself, by nlme, as JSON.
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))); source(file.path(here, "shared.R"))
needed("nlme", "jsonlite"); suppressMessages(library(nlme))

tight <- glsControl(tolerance = 1e-12, msTol = 1e-14, maxIter = 500, msMaxIter = 500, opt = "nlminb", returnObject = TRUE)
told <- function(d) {
  kind <- as.character(d$kind[1])
  fit <- tryCatch(switch(kind,
    neighbours = gls(y ~ treatment, d, correlation = corAR1(form = ~ place), control = tight),
    apart = gls(y ~ treatment, d, weights = varIdent(form = ~ 1 | site), control = tight)), error = function(e) NULL)
  if (is.null(fit)) return(list(failed = TRUE))
  ratios <- if (kind == "apart") coef(fit$modelStruct$varStruct, unconstrained = FALSE, allCoef = TRUE) else numeric(0)
  list(failed = FALSE, criterion = as.numeric(-2 * logLik(fit)), fixed = plain(coef(fit)), errors = plain(sqrt(diag(vcov(fit)))),
    alike = if (kind == "neighbours") as.numeric(coef(fit$modelStruct$corStruct, unconstrained = FALSE)) else NULL,
    variances = plain(if (kind == "apart") (fit$sigma * ratios[levels(d$site)])^2 else fit$sigma^2))
}
answer(lapply(designs(), told))
