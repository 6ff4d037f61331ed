/** Fabrics of which every wire, switch, site and pad was listed, as compressed arrays. */
package padward.fabric.explicit;
