# Rscript make.R: simulates the tables beside it and writes expected.json.
source("polished.R"); set.seed(20310)
# Fruits of plants of seasons of varieties, of any number at each level.
house <- function(varieties, sd, sizes) do.call(rbind, lapply(seq_len(varieties), function(variety) {
  mean <- rnorm(1, 4, .8)
  do.call(rbind, lapply(seq_len(sample(sizes[[1]], 1)), function(season) {
    of_season <- mean + rnorm(1, 0, sd[1])
    do.call(rbind, lapply(seq_len(sample(sizes[[2]], 1)), function(plant) {
      n <- sample(sizes[[3]], 1)
      data.frame(variety = sprintf("v%02d", variety), outer = sprintf("v%02d-s%d", variety, season), inner = sprintf("p%d", plant),
        y = round(of_season + rnorm(1, 0, sd[2]) + rnorm(n, 0, sd[3]), 4))
    }))
  }))
}))
plots <- do.call(rbind, lapply(1:9, function(block) { of_block <- rnorm(1, 0, 3)
  do.call(rbind, lapply(seq_len(sample(2:6, 1)), function(plot) { n <- sample(1:5, 1); x <- round(runif(n, 0, 10), 2)
    data.frame(variety = "v01", outer = sprintf("b%d", block), inner = sprintf("p%d", plot), x = x, y = round(50 + 1.7 * x + of_block + rnorm(1, 0, 2) + rnorm(n, 0, 1.5), 3)) })) }))
tables <- list(
  house = house(14, c(.27, .22, .31), list(1:4, 1:4, 1:6)),
  small_house = house(4, c(.3, .2, .3), list(2:3, 1:3, 1:3)),
  no_season_house = house(10, c(0, .1, .3), list(1:3, 2:3, 2:4)),
  plots = plots)
fixed <- list(house = "0 + variety", small_house = "0 + variety", no_season_house = "0 + variety", plots = "x")
for (name in names(tables)) write.csv(tables[[name]], paste0(name, ".csv"), row.names = FALSE, quote = FALSE)
fits <- lapply(setNames(names(tables), names(tables)), function(name) list(
  restricted = told(fixed[[name]], tables[[name]]), full = told(fixed[[name]], tables[[name]], REML = FALSE)))
write_json(list(software = list(R = as.character(getRversion()), lme4 = as.character(packageVersion("lme4"))), fits = fits),
  "expected.json", auto_unbox = TRUE, digits = I(12), pretty = TRUE, na = "null")
for (name in names(fits)) print(c(nrow(tables[[name]]), fits[[name]]$restricted$components, fits[[name]]$restricted$component_errors, fits[[name]]$restricted$last_newton_step, fits[[name]]$full$components))
