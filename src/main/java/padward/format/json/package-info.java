/** Streams of JSON with checked values: what all formats of ours are read and written with. */
package padward.format.json;
