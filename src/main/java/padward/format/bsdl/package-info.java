/** Package pins and directions of ports from files in BSDL (IEEE 1149.1). */
package padward.format.bsdl;
