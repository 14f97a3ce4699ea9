/**
 * The command line: arguments, clock, streams and exit codes, and nothing else. What may not depend on the moment or
 * the terminal is done below.
 */
package org.wearledger.cli;
