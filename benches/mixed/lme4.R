# Times lme4 on tables that crates/statistics/benches/large_trials.rs wrote: Rscript lme4.R FOLDER TRIAL
suppressMessages(library(lme4))
arguments <- commandArgs(TRUE)
table <- read.csv(file.path(arguments[1], paste0(arguments[2], ".csv")), stringsAsFactors = TRUE)
told <- function(name, seconds, fit) {
  parts <- as.data.frame(VarCorr(fit))
  cat(sprintf("lme4 %s: %.4f s, criterion %.6f\n", name, seconds, REMLcrit(fit)))
  cat(sprintf("  %s: %.7f\n", parts$grp, parts$vcov), sep = "")
}
if (arguments[2] == "small") {
  models <- list("varieties fixed" = yield ~ variety + site + (1 | block),
                 "varieties random" = yield ~ site + (1 | variety) + (1 | block))
  for (name in names(models)) {
    fit <- suppressMessages(lmer(models[[name]], table))
    began <- proc.time()[["elapsed"]]
    for (again in 1:50) fit <- suppressMessages(lmer(models[[name]], table))
    told(paste("72 plots,", name, "each"), (proc.time()[["elapsed"]] - began) / 50, fit)
  }
} else {
  control <- lmerControl(calc.derivs = FALSE)
  began <- proc.time()[["elapsed"]]
  fit <- lmer(yield ~ 1 + (1 | variety) + (1 | variety:site) + (1 | block) + (1 | site), table, control = control)
  told(paste(nrow(table), "plots"), proc.time()[["elapsed"]] - began, fit)
}
