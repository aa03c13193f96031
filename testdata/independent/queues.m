% Values of testdata/published/queues.csv worked out again by Octave's queueing package (Debian's octave and octave-queueing), one a line:
% its id and the number. Nothing here was taken from the table: each line states the model in the package's own terms.
1;

function say (id, x)
  printf ("%s %.12g\n", id, x);
end

% both waits, contents: of a queue with mean W and L in all, service mean s
function single (id, W, L, lambda, s)
  say ([id "_W"], W); say ([id "_L"], L);
  say ([id "_Wq"], W - s); say ([id "_Lq"], L - lambda * s);
end

% N machines that run for a mean time up, R menders with a mean repair of down: a closed network of as many servers as machines, and R of them
function repairman (id, N, R, up, down)
  [U, W, L, X] = qncsmva (N, [up down], [1 1], [N R]);
  say ([id "_run"], L(1)); say ([id "_X"], X(2)); say ([id "_W"], W(2));
  say ([id "_Lq"], L(2) - X(2) * down); say ([id "_lossm"], (L(2) - X(2) * down) / N);
  say ([id "_idle"], 1 - X(2) * down / R);
end

pkg load queueing

for rho = [0.5 0.8 0.9]
  [U, W, L] = qsmm1 (rho, 1);
  single (sprintf ("mm1_%g", rho), W, L, rho, 1);
  say (sprintf ("mm1_%g_PW5", rho), exp (-5 / W)); % the time in the system is exponential
end

for x = {{1.6, 2}, {2.4, 3}, {4, 5}, {9, 10}}
  lambda = x{1}{1}; c = x{1}{2};
  [U, W, L] = qsmmm (lambda, 1, c);
  single (sprintf ("mmc_%g_%d", lambda, c), W, L, lambda, 1);
end

for s = 1:2 % patients an hour; the table is in seconds
  [U, W, L, X, p0] = qsmmm (2, 3, s);
  id = sprintf ("hosp_s%d", s);
  say ([id "_L"], L); say ([id "_Lq"], L - 2/3); say ([id "_W"], 3600 * W); say ([id "_Wq"], 3600 * (W - 1/3)); say ([id "_p0"], p0);
end

for x = {{0.9, 1, 4}, {1, 1, 4}, {1.2, 1, 5}, {1.2, 2, 5}, {2, 2, 4}, {3, 3, 10}}
  [lambda, c, K] = x{1}{:};
  [U, W, L, X, p0, pK] = qsmmmk (lambda, 1, c, K);
  id = sprintf ("mmck_%g_%d_%d", lambda, c, K);
  say ([id "_PK"], pK); say ([id "_X"], X); say ([id "_L"], L); say ([id "_W"], W);
end

for x = {{0, "0"}, {1/2, "0.5"}, {1/4, "0.25"}, {2, "2"}, {4, "4"}, {1/12, "0.0833"}}
  [scv, name] = x{1}{:};
  for lambda = [0.5 0.8 0.9]
    [U, W, L] = qsmg1 (lambda, 1, 1 + scv);
    single (sprintf ("mg1_%g_%s", lambda, name), W, L, lambda, 1);
  end
end

% a station that breaks down every 20 busy s on average, for 5 s: its completion times have mean 5/4 and these variances
for x = {{"compl_1_0_20", 2.5}, {"compl_1_1_20", 2.5 + 1 / 0.8^2}}
  [id, variance] = x{1}{:};
  [U, W] = qsmg1 (0.6, 1.25, variance + 1.25^2);
  say ([id "_Wq"], W - 1.25); say ([id "_A"], 1 / 1.25);
end

repairman ("feller6_1", 6, 1, 10, 1);
repairman ("feller20_3", 20, 3, 10, 1);
repairman ("winston5_2", 5, 2, 30, 3);
repairman ("copy5_1", 5, 1, 2.5, 0.4);
repairman ("r4_1", 4, 1, 5, 1);
repairman ("r4_2", 4, 2, 5, 1);
repairman ("r6_2", 6, 2, 10, 2);

[U, W, L] = qnos (1, [1/2 2/3 4/5], [1 1 1]);
say ("jackson_L1", L(1)); say ("jackson_L2", L(2)); say ("jackson_L3", L(3)); say ("jackson_W", sum (W));

for N = [1 2 5]
  [U, W, L, X] = qncsmva (N, [1 1], [1 1]);
  say (sprintf ("conwip_2_%d", N), X(1));
end
