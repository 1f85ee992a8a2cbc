#!/usr/bin/env Rscript
# Fits the same rates with an independent library (lme4, Debian's r-cran-lme4).
#
# Usage: scripts/check_population_glmm.R
# Reads data/quarterbacks/quarterback_games.csv.gz; writes data/quarterbacks/glmm_check.csv: means
# by season and standard deviations of quarterback-seasons and opponent-seasons, Laplace, maximum
# likelihood. scripts/check_population.py --glmm puts ours beside them.
suppressPackageStartupMessages(library(lme4))

here <- dirname(sub("--file=", "", grep("--file=", commandArgs(FALSE), value = TRUE)))
folder <- file.path(here, "..", "data", "quarterbacks")
games <- read.csv(gzfile(file.path(folder, "quarterback_games.csv.gz")))
games$unit <- games$quarterback * 10000 + games$season

# The opponent is the other side's passer of that season; with three passers nobody is named.
in_game <- ave(games$unit, games$game, FUN = length)
other <- ave(games$unit, games$game, FUN = sum) - games$unit
games$opponent <- ifelse(in_game == 2, other, -seq_len(nrow(games)))
games <- games[ave(games$dropbacks, games$unit, FUN = sum) >= 100, ]
games$row <- seq_len(nrow(games))

deep <- function(what) rowSums(games[paste0("deep_", c("left", "middle", "right", "lane_unknown"),
                                            "_", what)])
rates <- list(
  completion = list(games$completions, games$attempts),
  sack = list(games$sacks, games$dropbacks),
  scramble = list(games$scrambles, games$dropbacks),
  completion_deep = list(deep("completions"), deep("attempts")))

fit <- function(name, with_game) {
  data <- data.frame(hits = rates[[name]][[1]], trials = rates[[name]][[2]],
                     season = factor(games$season), unit = factor(games$unit),
                     opponent = factor(games$opponent), row = factor(games$row))
  data <- data[data$trials > 0, ]
  formula <- cbind(hits, trials - hits) ~ 0 + season + (1 | unit) + (1 | opponent)
  if (with_game) formula <- update(formula, . ~ . + (1 | row))
  model <- glmer(formula, data, family = binomial,
                 control = glmerControl(optimizer = "bobyqa", calc.derivs = FALSE,
                                        optCtrl = list(maxfun = 20000)))
  spread <- function(what) attr(VarCorr(model)[[what]], "stddev")
  means <- fixef(model)
  errors <- sqrt(diag(as.matrix(vcov(model, use.hessian = FALSE))))
  rbind(
    data.frame(rate = name, game_effect = as.integer(with_game),
               quantity = sub("season", "mean_", names(means)),
               estimate = means, standard_error = errors),
    data.frame(rate = name, game_effect = as.integer(with_game),
               quantity = c("spread_quarterback", "spread_opponent", if (with_game) "spread_game"),
               estimate = c(spread("unit"), spread("opponent"), if (with_game) spread("row")),
               standard_error = NA),
    data.frame(rate = name, game_effect = as.integer(with_game), quantity = "log_likelihood",
               estimate = as.numeric(logLik(model)), standard_error = NA))
}

out <- do.call(rbind, lapply(names(rates), function(name) rbind(fit(name, FALSE), fit(name, TRUE))))
out$estimate <- signif(out$estimate, 7)
out$standard_error <- signif(out$standard_error, 5)
write.csv(out, file.path(folder, "glmm_check.csv"), row.names = FALSE, quote = FALSE, na = "")
print(out[!grepl("mean_", out$quantity), ], row.names = FALSE)
