/** Whether a design changed as its ledger says: differences, the audit, newer runs. */
package padward.breakout.verify;
