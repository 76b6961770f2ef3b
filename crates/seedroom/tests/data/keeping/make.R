# The decline of lots in storage, fitted by R's glm: probit regression of counts on days. Prints one line a lot of expected.csv.
# Rscript make.R > expected.csv
options(digits = 15)
lots <- list(
  list(d = c(30, 400, 760, 1130), y = c(380, 368, 340, 301), n = c(400, 400, 400, 400)),
  list(d = c(20, 380), y = c(97, 88), n = c(100, 100)),
  list(d = c(14, 200, 365), y = c(196, 190, 181), n = c(200, 200, 200)),
  list(d = c(60, 420, 800), y = c(50, 47, 41), n = c(50, 50, 50)),
  list(d = c(10, 10, 375, 740), y = c(92, 95, 87, 70), n = c(100, 100, 100, 100)),
  list(d = c(30, 395, 760, 1125, 1490, 1855), y = c(384, 380, 365, 342, 290, 231), n = rep(400, 6)),
  list(d = c(0, 500, 1000), y = c(360, 361, 359), n = rep(400, 3)),
  list(d = c(100, 900, 1700), y = c(24, 20, 11), n = c(25, 25, 25)),
  list(d = c(45, 410, 775), y = c(388, 300, 120), n = rep(400, 3)),
  list(d = c(30, 60, 90, 120, 150, 180, 210, 240), y = c(99, 98, 96, 97, 93, 94, 90, 88), n = rep(100, 8))
)
cat("lot,days,normal,sown,start,start_se,a_day,a_day_se,both,deviance,days_to_75\n")
for (i in seq_along(lots)) {
  l <- lots[[i]]
  m <- glm(cbind(l$y, l$n - l$y) ~ l$d, family = binomial(link = "probit"),
           control = glm.control(epsilon = 1e-14, maxit = 200))
  b <- unname(coef(m)); v <- unname(vcov(m))
  to75 <- (qnorm(0.75) - b[1]) / b[2]
  cat(i, paste(l$d, collapse = " "), paste(l$y, collapse = " "), paste(l$n, collapse = " "),
      sprintf("%.12g", b[1]), sprintf("%.12g", sqrt(v[1, 1])), sprintf("%.12g", b[2]), sprintf("%.12g", sqrt(v[2, 2])),
      sprintf("%.12g", v[1, 2]), sprintf("%.12g", deviance(m)), sprintf("%.12g", to75), sep = ",")
  cat("\n")
}
