/**
 * Netlists of other tools: structural Verilog (IEEE 1364) and EDIF 2 0 0, flattened and turned into
 * cells of a fabric's kinds by a mapping.
 */
package padward.format.netlist;
