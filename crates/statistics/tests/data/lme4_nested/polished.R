# Polished lme4 fits of nested models, shared by make.R (frozen values) and live.R (values of this machine).
suppressMessages({library(lme4); library(numDeriv); library(jsonlite)})

# An lmer fit whose theta is moved to the optimum by Newton steps on Richardson derivatives of the deviance;
# components on the boundary stay there. lme4's own stop is too early to compare eight digits with.
polished <- function(formula, data, REML = TRUE) {
  parts <- lFormula(formula, data, REML = REML, control = lmerControl(
    check.nobs.vs.nRE = "ignore", check.nobs.vs.nlev = "ignore", check.nlev.gtr.1 = "ignore"))
  deviance <- do.call(mkLmerDevfun, parts)
  theta <- nloptwrap(par = parts$reTrms$theta, fn = deviance, lower = parts$reTrms$lower,
    upper = rep(Inf, length(parts$reTrms$theta)),
    control = list(xtol_abs = 1e-10, ftol_abs = 1e-11, maxeval = 5000))$par
  free <- which(theta > 1e-3); theta[setdiff(seq_along(theta), free)] <- 0
  along <- function(x) { moved <- theta; moved[free] <- x; deviance(moved) }
  step <- 0
  if (length(free)) for (i in 1:4) {
    step <- solve(hessian(along, theta[free]), grad(along, theta[free]))
    theta[free] <- theta[free] - step
    if (max(abs(step)) < 1e-9) break
  }
  value <- deviance(theta) # the last evaluation sets the state that the fit is made from
  fit <- mkMerMod(environment(deviance), list(par = theta, fval = value, conv = 0, feval = 0, message = ""),
    parts$reTrms, fr = parts$fr, mc = quote(lmer()))
  attr(fit, "last_newton_step") <- max(abs(step)); fit
}

# Average information of (outer, inner, residual) from dense matrices; rows of zero components are left out.
average_information_errors <- function(y, X, outer, inner, v) {
  levels <- list(tcrossprod(model.matrix(~ 0 + outer)), tcrossprod(model.matrix(~ 0 + inner)), diag(length(y)))
  Vi <- solve(v[1] * levels[[1]] + v[2] * levels[[2]] + v[3] * levels[[3]])
  P <- Vi - Vi %*% X %*% solve(t(X) %*% Vi %*% X, t(X) %*% Vi)
  W <- sapply(levels, function(L) L %*% (P %*% y)); keep <- which(v > 0)
  errors <- rep(NA, 3); errors[keep] <- sqrt(diag(solve((t(W) %*% P %*% W / 2)[keep, keep]))); errors
}

# Everything that the Rust test compares, for columns y, outer, inner and a fixed-effects formula.
told <- function(fixed, data, REML = TRUE) {
  data$outer <- factor(data$outer); data$inner <- factor(paste(data$outer, data$inner))
  if (!is.null(data$variety)) data$variety <- factor(data$variety)
  fit <- polished(as.formula(paste("y ~", fixed, "+ (1 | outer) + (1 | inner)")), data, REML)
  components <- as.data.frame(VarCorr(fit)); v <- setNames(components$vcov, components$grp)[c("outer", "inner", "Residual")]
  list(model = paste("y ~", fixed, "+ (1 | outer / inner)"), restricted = REML,
    criterion = as.numeric(-2 * logLik(fit)), components = unname(v),
    component_errors = average_information_errors(data$y, getME(fit, "X"), data$outer, data$inner, unname(v)),
    fixed_effects = unname(fixef(fit)), fixed_effect_errors = unname(sqrt(diag(as.matrix(vcov(fit))))),
    outer_effects = as.list(setNames(ranef(fit)$outer[, 1], rownames(ranef(fit)$outer))),
    inner_effects = as.list(setNames(ranef(fit)$inner[, 1], rownames(ranef(fit)$inner))),
    last_newton_step = attr(fit, "last_newton_step"))
}
