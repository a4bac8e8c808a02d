"""Makes random fresh waters for the batch: python3 water-batch.py ROWS > waters.csv (kept seed)."""
import random,sys
random.seed(1)
n=int(sys.argv[1])
w=sys.stdout.write
w("id,temperature_c,na,k,ca,mg,nh4,cl,so4,no3,po4,alkalinity_meq_per_l,ph,dic_mmol_per_l\n")
u=random.uniform
for i in range(n):
    alk=u(0.2,6); 
    w("w%d,%.1f,%.1f,%.1f,%.1f,%.1f,%.2f,%.1f,%.1f,%.1f,%.2f,%.3f,%s\n"%(i,u(0,35),u(1,80),u(0,10),u(2,120),u(0.5,30),u(0,1),u(2,120),u(1,150),u(0,40),u(0,3),alk,("%.2f,"%u(6,8.8)) if i%2 else ",%.3f"%(alk*u(1.0,1.3))))
