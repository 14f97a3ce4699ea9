/**
 * Statistics on plain numbers: quartiles, the Theil-Sen line, rank sums; gamma processes with a random rate that drifts, means
 * drawn together, counts and amounts by probability; scores of forecasts. Here so that each formula can be read and held against
 * its published source without knowing anything of drives. Pure functions of their arguments; what cannot be worked out from
 * too few values is an empty {@code Optional} or NaN, as each says, never a guess.
 */
package org.wearledger.stats;
