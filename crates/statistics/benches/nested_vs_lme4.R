# Rscript nested_vs_lme4.R FOLDER: times lme4 on the two tables that the bench wrote to FOLDER
# (LOCULE_BENCH_TABLES=FOLDER cargo bench --profile release -p statistics). Run both at one sitting and compare.
suppressMessages(library(lme4))
folder <- tail(commandArgs(TRUE), 1)
for (name in c("plots_72", "rows_20000")) {
  table <- read.csv(file.path(folder, paste0(name, ".csv")), stringsAsFactors = TRUE)
  fit <- function() lmer(y ~ 0 + treatment + (1 | outer / inner), table)
  model <- fit() # the first fit also loads code
  times <- replicate(if (nrow(table) < 1000) 40 else 5, system.time(fit())[["elapsed"]])
  cat(sprintf("%s: median %.1f ms, best %.1f ms; criterion %.8f\n", name, 1000 * median(times), 1000 * min(times), -2 * logLik(model)))
}
