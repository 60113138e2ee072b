new PagefindUI({ element: "#wm-finder", showImages: false, resetStyles: false });
