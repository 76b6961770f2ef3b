# Rscript mixed.R TABLE.csv: treatments fixed, blocks and sites crossed at random, by lme4, lmerTest and pbkrtest, as JSON.
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))); source(file.path(here, "shared.R"))
needed("lme4", "lmerTest", "jsonlite"); suppressMessages({library(lme4); library(lmerTest)})

tight <- lmerControl(optimizer = "nloptwrap", calc.derivs = FALSE, check.conv.singular = "ignore",
  optCtrl = list(xtol_abs = 1e-11, ftol_abs = 1e-13, maxeval = 5000))
told <- function(d) {
  fit <- suppressMessages(suppressWarnings(lmerTest::lmer(y ~ treatment + (1 | block) + (1 | site), d, control = tight)))
  components <- as.data.frame(VarCorr(fit)); rows <- summary(fit)$coefficients[-1, , drop = FALSE]
  # Kenward and Roger's by pbkrtest, slow: of every fifth design.
  adjusted <- if (d$seed[1] %% 5 == 0 && requireNamespace("pbkrtest", quietly = TRUE)) summary(fit, ddf = "Kenward-Roger")$coefficients[-1, , drop = FALSE] else NULL
  list(adjusted_errors = if (is.null(adjusted)) NULL else plain(adjusted[, "Std. Error"]),
    adjusted_degrees = if (is.null(adjusted)) NULL else plain(adjusted[, "df"]), criterion = as.numeric(-2 * logLik(fit)), components = plain(setNames(components$vcov, components$grp)[c("block", "site", "Residual")]),
    differences = plain(rows[, "Estimate"]), errors = plain(rows[, "Std. Error"]), degrees = plain(rows[, "df"]))
}
answer(lapply(designs(), told))
