/**
 * Bytes to readings: finds report files, tells their format, flattens each record to dotted field names, converts the
 * fields once and says where it failed. JSON, CSV and the raw log page meet in {@link org.wearledger.intake.ReadingParser},
 * so that one report gives one reading whatever it was written in. Reads the side tables, the mapping and an earlier sweep's tables
 * too: no other package opens an input file.
 */
package org.wearledger.intake;
