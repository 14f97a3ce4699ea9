/**
 * One drive's history to consumed endurance, projection and standing, and the fleet's drives and machines compared;
 * pure; knows only model and stats.
 */
package org.wearledger.assess;
