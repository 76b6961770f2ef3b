# Rscript live.R TABLE.csv: fits y ~ 0 + variety + (1 | outer / inner) here and now, answers as JSON.
arguments <- commandArgs(); here <- dirname(sub("--file=", "", grep("--file=", arguments, value = TRUE)))
source(file.path(here, "polished.R"))
answer <- told("0 + variety", read.csv(tail(arguments, 1)))
cat(toJSON(answer, auto_unbox = TRUE, digits = I(12), na = "null"))
