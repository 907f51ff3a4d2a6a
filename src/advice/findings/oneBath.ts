export const ONE_BATH =
  "One bath gives no trend; the range for the next is ninefold. A second short bath (2 minutes) or a blotter test tells more than another full one.";
