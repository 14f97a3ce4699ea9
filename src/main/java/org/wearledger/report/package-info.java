/**
 * Turns a finished sweep, a backtest or a machine's story into the files people open: a workbook, CSV tables, a plain-text
 * summary, a page. Each table is defined once as a {@link org.wearledger.report.Table} and feeds both CSV and XLSX; nothing here
 * computes wear or reads a clock. Rated figures that rest on the rule of thumb carry the word "assumed" wherever they are shown.
 */
package org.wearledger.report;
