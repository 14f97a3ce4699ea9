/**
 * From loose readings to one history per drive: which readings are kept, which are set aside by a named rule, where
 * counters started again, and which drive sits in which machine. Pure: knows only {@code model} and the JDK, and gives
 * the same outcome whatever the order of its input.
 */
package org.wearledger.history;
