/** Names of columns that hold the cold end of the thermocouples, or how warm the logger is inside. */
export const COLD_END =
  /(?:^|[^a-zäöüéè])(?:cj|cjc|cjt|rj|cold[ _-]?(?:junction|end)|ref(?:erence)?[ _-]?junction|board[ _-]?temp\w*|internal[ _-]?temp\w*|logger[ _-]?temp\w*|device[ _-]?temp\w*|vergleichsstelle)(?:[^a-zäöüéè]|$)/i;
