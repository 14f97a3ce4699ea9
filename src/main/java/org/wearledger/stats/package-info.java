/**
 * Robust statistics on plain numbers: quartiles, the Theil-Sen line, the rank-sum comparison and Holm's correction.
 * Pure functions of their arguments that know nothing of drives. Each names its method and published source; what
 * cannot be worked out from too few values is an empty {@code Optional}, never a guess.
 */
package org.wearledger.stats;
