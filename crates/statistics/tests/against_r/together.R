# Rscript together.R TABLE.csv: treatments in blocks by lm, then Dunnett's and Tukey's p values, as JSON.
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))); source(file.path(here, "shared.R"))
needed("multcomp", "mvtnorm", "jsonlite"); suppressMessages(library(multcomp)); set.seed(1)

told <- function(d) {
  fit <- lm(y ~ treatment + block, d); k <- nlevels(d$treatment); own <- 2:k
  b <- coef(fit)[own]; V <- vcov(fit)[own, own, drop = FALSE]
  p <- summary(glht(fit, linfct = mcp(treatment = "Dunnett"), alternative = as.character(d$kind[1])),
    test = adjusted("single-step", abseps = 1e-5, maxpts = 5e5))$test$pvalues
  m <- c(0, b); W <- rbind(0, cbind(0, V)); pairs <- combn(k, 2)
  t <- apply(pairs, 2, function(p) (m[p[1]] - m[p[2]]) / sqrt(W[p[1], p[1]] + W[p[2], p[2]] - 2 * W[p[1], p[2]]))
  list(means = plain(m), covariance = lapply(seq_len(k), function(i) plain(W[i, ])), degrees = df.residual(fit),
    check = plain(p),
    pairs = plain(ptukey(sqrt(2) * abs(t), k, df.residual(fit), lower.tail = FALSE)))
}
answer(lapply(designs(), told))
