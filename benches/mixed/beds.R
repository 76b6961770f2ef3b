# Times mgcv and nlme on beds that crates/statistics/benches/beds.rs wrote: Rscript beds.R FOLDER ROWSxCOLUMNS
# mgcv fits the same surface (five penalised parts, random rows, columns and varieties), so that criteria can be set side by side;
# nlme has no separable autoregression over rows and columns: it fits an exponential correlation with a nugget and no varieties.
suppressMessages({ library(mgcv); library(nlme) })
arguments <- commandArgs(TRUE)
table <- read.csv(file.path(arguments[1], paste0("bed-", arguments[2], ".csv")), stringsAsFactors = TRUE)
axis <- function(x, segments) {
  step <- diff(range(x)) / segments
  knots <- seq(min(x) - 3 * step, max(x) + 3 * step, by = step)
  bases <- splines::splineDesign(knots, x, ord = 4, outer.ok = TRUE)
  parts <- eigen(crossprod(diff(diag(ncol(bases)), differences = 2)), TRUE)
  kept <- seq_len(ncol(bases) - 2)
  list(bases = bases %*% parts$vectors[, kept], penalty = parts$values[kept])
}
share <- function(x) (x - min(x)) / diff(range(x))
divided <- function(bases, by) sweep(bases, 2, sqrt(by), "/")
r <- share(table$row); c <- share(table$column)
down <- axis(table$row, 10); across <- axis(table$column, 8)
sum_of <- outer(across$penalty, down$penalty, "+")
both <- down$bases[, rep(seq_len(ncol(down$bases)), each = ncol(across$bases))] *
  across$bases[, rep(seq_len(ncol(across$bases)), ncol(down$bases))]
data <- list(y = table$yield, X = cbind(r, c, r * c), V = model.matrix(~ 0 + variety, table),
             R = model.matrix(~ 0 + factor(row), table), C = model.matrix(~ 0 + factor(column), table),
             S1 = divided(down$bases, down$penalty), S2 = divided(across$bases, across$penalty),
             S3 = c * divided(down$bases, down$penalty), S4 = r * divided(across$bases, across$penalty),
             S5 = divided(both, as.vector(sum_of)))
terms <- c("V", "R", "C", paste0("S", 1:5))
penalties <- setNames(lapply(terms, function(name) list(diag(ncol(data[[name]])))), terms)
began <- proc.time()[["elapsed"]]
fit <- gam(y ~ X + V + R + C + S1 + S2 + S3 + S4 + S5, paraPen = penalties, data = data, method = "REML")
cat(sprintf("mgcv %s plots, surface: %.3f s, criterion %.6f\n", arguments[2], proc.time()[["elapsed"]] - began,
            2 * as.numeric(fit$gcv.ubre)))
if (nrow(table) <= 400) {
  began <- proc.time()[["elapsed"]]
  fit <- gls(yield ~ 1, table, correlation = corExp(c(3, 0.3), form = ~ row + column, nugget = TRUE), method = "REML")
  cat(sprintf("nlme %s plots, neighbours without varieties: %.3f s, criterion %.6f\n", arguments[2],
              proc.time()[["elapsed"]] - began, -2 * as.numeric(logLik(fit))))
}
