package org.wearledger.planted.stray;

/** In a package that is no layer. */
final class BelongsNowhere {
}
