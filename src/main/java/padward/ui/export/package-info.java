/** Pictures and tables of what the window shows, saved as files. */
package padward.ui.export;
