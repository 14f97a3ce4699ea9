/**
 * What the histories say: one drive's consumed endurance, forecasts and standing, the wear model of the fleet that they rest on
 * and its backtest, and drive models and memory sizes compared. Here are the trade's rules; the formulas behind them are in
 * {@code stats}. Pure: knows only {@code model} and {@code stats}.
 */
package org.wearledger.assess;
