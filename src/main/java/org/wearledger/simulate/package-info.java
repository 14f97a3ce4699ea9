/**
 * Makes the sample reports: an invented office, swept once a quarter, with every fault a reader of real exports meets.
 * Also draws fleets of any size from stated distributions, with the truth beside the reports: real fleets that may be shown to
 * everybody, and whose future is known, do not exist. The same seed gives the same bytes. Knows {@code model}, Jackson,
 * Commons CSV and Commons Math only.
 */
package org.wearledger.simulate;
